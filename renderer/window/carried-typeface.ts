/** The drawing's typeface as text, for files that have to look the same anywhere. */
import boldAddress from "../../assets/fonts/drawing-bold.woff2?url";
import regularAddress from "../../assets/fonts/drawing-regular.woff2?url";

const ADDRESSES = { regular: regularAddress, bold: boldAddress } as const;

/** Base64 of the woff2 file. */
export async function carriedTypeface(weight: keyof typeof ADDRESSES): Promise<string> {
  const bytes = new Uint8Array(await (await fetch(ADDRESSES[weight])).arrayBuffer());
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
}
