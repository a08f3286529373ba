/** The shipped typeface, put in by the build (build.mjs), so that a sheet looks the same on every machine. */
declare const TYPEFACE_BASE64: string | undefined;

export const TYPEFACE: { readonly format: "woff2"; readonly base64: string } | undefined =
  typeof TYPEFACE_BASE64 === "string" ? { format: "woff2", base64: TYPEFACE_BASE64 } : undefined;
