/** From the bytes of a file to its text: size and encoding are looked at before anything else. */
import { LIMITS } from "./limits.ts";

export type Decoded =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly string[] };

/** The sentence for a file beyond the limit; also for a caller that knows the size before reading the bytes. */
export function tooLarge(bytes: number): string | undefined {
  if (bytes <= LIMITS.bytes) return undefined;
  return (
    `The file is ${Math.ceil(bytes / 1e6)} MB long; a project or wire list may have at most ${LIMITS.bytes / 1e6} MB. ` +
    `Choose another file, or split the drawing.`
  );
}

/** Where bytes stop being UTF-8 (RFC 3629), as an index, or undefined. */
function firstNotUtf8(bytes: Uint8Array): number | undefined {
  let at = 0;
  while (at < bytes.length) {
    const lead = bytes[at] ?? 0;
    const more = lead < 0x80 ? 0 : lead >= 0xc2 && lead < 0xe0 ? 1 : lead >= 0xe0 && lead < 0xf0 ? 2 : 3;
    if ((lead >= 0x80 && lead < 0xc2) || lead > 0xf4) return at;
    for (let next = 1; next <= more; next += 1) {
      const byte = bytes[at + next] ?? 0;
      // The second byte also rules out over-long forms, surrogates and what lies beyond U+10FFFF.
      const least = next > 1 ? 0x80 : lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
      const most = next > 1 ? 0xbf : lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
      if (byte < least || byte > most) return at;
    }
    at += more + 1;
  }
  return undefined;
}

/**
 * The text of a file that should be UTF-8, without its byte order mark.
 * @param decode turns UTF-8 bytes into text; handed in, because the core has no decoder of its own
 */
export function decodeUtf8(bytes: Uint8Array, decode: (bytes: Uint8Array) => string): Decoded {
  const refuse = (problem: string): Decoded => ({ ok: false, problems: [problem] });
  const long = tooLarge(bytes.length);
  if (long !== undefined) return refuse(long);
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return refuse("The file is saved as UTF-16 text. Save it again as UTF-8.");
  }
  const wrong = firstNotUtf8(bytes);
  if (wrong !== undefined) {
    let line = 1;
    for (let at = 0; at < wrong; at += 1) if (bytes[at] === 0x0a) line += 1;
    return refuse(
      `Line ${line} of the file holds characters that are not UTF-8 text. Save it again as UTF-8, or choose another file.`,
    );
  }
  const text = decode(bytes);
  return { ok: true, text: text.startsWith("\uFEFF") ? text.slice(1) : text };
}
