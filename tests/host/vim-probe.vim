" Writes a line of JSON for each line of a file: where in it which syntax group begins, counted in bytes.
set nomodeline noswapfile viminfo= encoding=utf-8 fileencodings=utf-8 fileformats=unix
let &runtimepath = $UNGULA_VIM . ',' . &runtimepath
filetype on
syntax on
execute 'edit' fnameescape($UNGULA_LINES)
let s:answer = [json_encode({ 'filetype': &filetype, 'syntax': get(b:, 'current_syntax', '') })]
for s:line in range(1, line('$'))
  let s:runs = []
  let s:last = ''
  for s:column in range(1, len(getline(s:line)))
    let s:group = synIDattr(synID(s:line, s:column, 1), 'name')
    if s:group !=# s:last
      call add(s:runs, [s:column - 1, s:group])
      let s:last = s:group
    endif
  endfor
  call add(s:answer, json_encode(s:runs))
endfor
call writefile(s:answer, $UNGULA_ANSWER)
qall!
