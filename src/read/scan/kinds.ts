/** Pictures told by their first bytes. */

export function isPng(bytes: Uint8Array): boolean {
  return [0x89, 0x50, 0x4e, 0x47].every((byte, i) => bytes[i] === byte);
}

export function isJpeg(bytes: Uint8Array): boolean {
  return bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff;
}
