export const crooked   = { a:1,
    b :2 }
