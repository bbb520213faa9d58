/** Of the program; the same as in package.json, which a test holds it to. */
export const version = '1.0.0';
