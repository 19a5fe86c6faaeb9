" Made by scripts/colours.ts.
au BufRead,BufNewFile *.hoof setfiletype hoof
