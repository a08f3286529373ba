/** The program's version, as in package.json (a test holds them equal). */
export const VERSION = "0.1.0";
