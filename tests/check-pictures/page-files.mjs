/** Every file of assets/check-pages by its name: a page and two pictures a check, and what the pictures show in words. */
/**
 * @param {typeof import("./picture-pages.ts")} pictures as `load.mjs` loads it
 * @returns {ReadonlyMap<string, string>}
 */
export function checkPageFiles({ CHECKS, checkPage, picturesOf }) {
  /** @type {Map<string, string>} */
  const files = new Map();
  /** @type {Record<string, import("../../core/checks/page.ts").PictureTexts>} */
  const texts = {};
  for (const check of CHECKS) {
    const pictures = picturesOf(check.id);
    files.set(`${check.id}.md`, checkPage(check, pictures.texts));
    files.set(`${check.id}-wrong.svg`, pictures.wrong);
    files.set(`${check.id}-right.svg`, pictures.right);
    texts[check.id] = pictures.texts;
  }
  files.set("pictures.json", `${JSON.stringify(texts, null, 2)}\n`);
  return files;
}
