async function later(): Promise<number> {
  return await Promise.resolve(1);
}
later();

type Signal = "red" | "green";
export function word(signal: Signal): string {
  switch (signal) {
    case "red":
      return "stop";
  }
  return "";
}

// eslint-disable-next-line
export const hidden: any = 2;

// @ts-ignore
export const anything: number = "1";

export default word;
