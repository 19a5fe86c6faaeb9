/** Today by the clock of whoever writes, `YYYY-MM-DD`. */
export function dayHere(): string {
  const now = new Date();
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
