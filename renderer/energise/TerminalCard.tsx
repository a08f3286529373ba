export function TerminalCard() {
  return null;
}
