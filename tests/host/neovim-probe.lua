-- Run by neovim.ts inside a Neovim without any configuration. Everything between the editor and the server is the
-- editor's own client; what it then shows is written down as JSON.
local task = vim.fn.json_decode(vim.env.UNGULA_TASK)
local patience = 20000

vim.cmd('filetype on')
dofile(vim.fn.has('nvim-0.11') == 1 and task.guide.current or task.guide.older)
vim.cmd('edit ' .. vim.fn.fnameescape(task.case))
local buffer = vim.api.nvim_get_current_buf()

-- The editor counts bytes, the command line UTF-16 units.
local function place(line, byte)
  local text = vim.api.nvim_buf_get_lines(buffer, line, line + 1, false)[1] or ''
  local _, units = vim.str_utfindex(text, math.min(byte, #text))
  return units + 1
end

local severities = { 'error', 'warning', 'info', 'hint' }

local function shown()
  return vim.tbl_map(function(one)
    return {
      line = one.lnum + 1,
      column = place(one.lnum, one.col),
      severity = severities[one.severity],
      code = one.code,
      message = one.message,
    }
  end, vim.diagnostic.get(buffer))
end

-- More than one round may be needed until the server has looked at the pictures: the count says which is awaited, and
-- where it never comes the last state is written down for the comparison to fail on.
local function findings(count, before)
  vim.wait(patience, function()
    local now = shown()
    return #now == count and not vim.deep_equal(now, before)
  end, 20)
  return shown()
end

local function ask(method, position)
  local params = { textDocument = { uri = vim.uri_from_bufnr(buffer) }, position = position }
  local answers = vim.lsp.buf_request_sync(buffer, method, params, patience) or {}
  local _, answer = next(answers)
  return answer and answer.result or vim.NIL
end

local clients = vim.lsp.get_clients or vim.lsp.get_active_clients
local answer = { version = tostring(vim.version().major) .. '.' .. tostring(vim.version().minor) }
answer.opened = findings(task.opened, {})
answer.clients = #clients()
answer.hover = ask('textDocument/hover', task.hover)
answer.completion = ask('textDocument/completion', task.completion)

local edit = task.edit
vim.api.nvim_buf_set_text(buffer, edit.line, edit.from, edit.line, edit.to, { edit.text })
answer.edited = findings(task.edited, answer.opened)

vim.lsp.stop_client(clients())
answer.ended = vim.wait(patience, function()
  return #clients() == 0
end, 20)

vim.fn.writefile({ vim.fn.json_encode(answer) }, task.answer)
