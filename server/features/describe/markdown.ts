/** Text of the user's own inside a line, shown as it is, whatever signs it holds. */
export function plain(text: string): string {
  return text.replace(/[\\`*_[\]<>|~&]/g, '\\$&').replace(/\s+/g, ' ');
}

export function code(text: string): string {
  return `\`${text}\``;
}

/** Lines of the notation, coloured by the client. */
export function notation(...lines: string[]): string {
  return ['```hoof', ...lines, '```'].join('\n');
}

export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replace(/(?<!\\)\|/g, '\\|')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

export function paragraphs(...parts: readonly (string | null | undefined | false)[]): string {
  return parts.filter((part) => typeof part === 'string' && part !== '').join('\n\n');
}
