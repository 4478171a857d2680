// Photos from the tablet's camera, made small before they travel: a shop's Wi-Fi is slow and the server takes 12 MiB.

const longestSide = 1920;
const quality = 0.82;

/** Scaled down to at most 1920 px as JPEG; the file as it is when the browser can not draw it. */
export async function shrink(file: File): Promise<Blob> {
  if (file.type === 'application/pdf' || typeof createImageBitmap === 'undefined') return file;
  const bitmap = await createImageBitmap(file).catch(() => null);
  if (!bitmap) return file;
  const share = Math.min(1, longestSide / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * share));
  canvas.height = Math.max(1, Math.round(bitmap.height * share));
  const context = canvas.getContext('2d');
  if (!context) return file;
  context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const small = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', quality));
  return small ?? file;
}
