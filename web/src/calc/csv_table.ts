// A CSV file as a spreadsheet or a logger writes it: a line of names, and rows of cells as texts.

export interface CsvTable {
  names: string[];
  rows: string[][];
}

/** The separator is whichever of semicolon, tab and comma the first line has. */
function separatorOf(line: string): string {
  return [';', '\t', ','].find((s) => line.includes(s)) ?? ',';
}

/** Cells of a whole text; a cell in double quotes may hold the separator, line ends and doubled quotes. */
function cellsOf(text: string, separator: string): string[][] {
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  const endCell = () => {
    rows[rows.length - 1]?.push(cell.trim());
    cell = '';
  };
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') cell += text[++i];
      else quoted = false;
    } else if (c === '"' && cell.trim() === '') {
      cell = '';
      quoted = true;
    } else if (c === separator) endCell();
    else if (c === '\n') {
      endCell();
      rows.push([]);
    } else cell += c;
  }
  endCell();
  return rows.filter((row) => row.some((c) => c !== ''));
}

/** Null when there is no row below the names. */
export function parseCsv(text: string): CsvTable | null {
  const plain = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const [names, ...rows] = cellsOf(plain, separatorOf(plain.split('\n', 1)[0] ?? ''));
  return names && rows.length > 0 ? { names, rows } : null;
}

/** Of a column called "Q [gpm]" or "Q (gpm)": gpm. */
export const unitOfName = (name: string): string => /[[(]([^\])]*)[\])]\s*$/.exec(name)?.[1]?.trim() ?? '';
