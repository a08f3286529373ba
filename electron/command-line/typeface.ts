/** The shipped typeface, put in by the build (build.mjs), so that a sheet or report looks the same on every machine. */
declare const TYPEFACE_BASE64: string | undefined;
declare const TYPEFACE_BOLD_BASE64: string | undefined;

export const TYPEFACE: { readonly format: "woff2"; readonly base64: string } | undefined =
  typeof TYPEFACE_BASE64 === "string" ? { format: "woff2", base64: TYPEFACE_BASE64 } : undefined;

export const TYPEFACE_BOLD: string | undefined =
  typeof TYPEFACE_BOLD_BASE64 === "string" ? TYPEFACE_BOLD_BASE64 : undefined;
