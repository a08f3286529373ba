/** The window's own address, and what is served under it. */
import { answerFor } from "../web-server/page-files.mjs";

export const SCHEME = "app";
const HOST = "bundle";
export const PAGE = `${SCHEME}://${HOST}/index.html`;

/** Not by `origin`: Node calls that of a scheme of one's own "null". */
export function isOurs(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, host } = new URL(address);
  return protocol === `${SCHEME}:` && host === HOST;
}

/** @param folder absolute: the built window */
export async function answerPage(
  folder: string,
  request: { readonly url: string; readonly method: string },
): Promise<Response> {
  // Another host has no files: its answer still carries the strict policy.
  const address = isOurs(request.url) ? new URL(request.url).pathname : "/no-such-host";
  const { status, headers, body } = await answerFor(folder, request.method, address);
  return new Response(body, { status, headers });
}
