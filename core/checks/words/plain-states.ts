/** Short lists of states: where a plain state is named, the same state with one control moved says nothing more. */

/**
 * Names without those that begin with another name of the list: "parked with S1 on", "parked after driving" beside
 * "parked". An operating state's name holds no space, so that only such additions begin with one.
 */
export function plainStates(names: readonly string[]): readonly string[] {
  const all = new Set(names);
  return [...all].filter((name) => {
    const [plain = name] = name.split(" ", 1);
    return plain === name || !all.has(plain);
  });
}
