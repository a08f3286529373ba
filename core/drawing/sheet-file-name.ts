/** "02-power-side": a sheet's place in the set (from 0) and its name, in letters that every file system takes. No ending. */
export function sheetFileName(index: number, name: string): string {
  const plain = name
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 60);
  const place = String(index + 1).padStart(2, "0");
  return plain === "" ? place : `${place}-${plain}`;
}
