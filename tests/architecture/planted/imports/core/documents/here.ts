export const here = "documents";
