/**
 * Lines of a text: from offsets to lines and columns and back, by the line ends of the language server protocol (LF, CRLF, CR).
 * Lines and columns here count from 0, columns in UTF-16 units; whoever shows them to a person adds 1.
 */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Lines {
  readonly count: number;
  /** Clamped to the text: any number in, a position inside the text out. */
  position(offset: number): Position;
  /** Clamped likewise; a column past the line's end gives the line's end. */
  offset(position: Position): number;
  /** The line's text without its end; empty outside the text. */
  text(line: number): string;
}

export function linesOf(text: string): Lines {
  const starts = [0];
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 13 && text.charCodeAt(at + 1) === 10) continue;
    if (code === 10 || code === 13) starts.push(at + 1);
  }
  const start = (line: number): number => starts[line] ?? text.length;
  const end = (line: number): number => {
    if (line + 1 >= starts.length) return text.length;
    const next = start(line + 1);
    return text.charCodeAt(next - 1) === 10 && text.charCodeAt(next - 2) === 13 ? next - 2 : next - 1;
  };
  return {
    count: starts.length,
    position: (offset) => {
      const at = clamp(offset, text.length);
      const line = lastAtMost(starts, at);
      return { line, character: at - start(line) };
    },
    offset: ({ line, character }) => {
      if (!(line >= 0)) return 0;
      if (line >= starts.length) return text.length;
      const row = Math.floor(line);
      return start(row) + clamp(character, end(row) - start(row));
    },
    text: (line) => (line >= 0 && line < starts.length ? text.slice(start(line), end(line)) : ""),
  };
}

function clamp(value: number, most: number): number {
  if (!(value > 0)) return 0;
  return Math.min(Math.floor(value), most);
}

function lastAtMost(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((sorted[middle] ?? 0) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
