/** Turns what the camera gave into a small upright JPEG without position data; the canvas keeps pixels only. */
import { heicSize, isHeic } from "./heic";

const LONGEST_EDGE_PX = 1600;
const THUMB_EDGE_PX = 160;
const TARGET_BYTES = 400_000;
const QUALITIES = [0.8, 0.7, 0.6, 0.5];
export const MOST_BYTES = 8_000_000;

export interface Shrunk {
  bytes: ArrayBuffer;
  mime: "image/jpeg" | "image/heic";
  width_px: number;
  height_px: number;
  thumb: ArrayBuffer | null;
}

/** `not_an_image`: neither this browser nor the server can open it. `too_large`: more than the server takes. */
export class PhotoRefused extends Error {
  constructor(readonly reason: "not_an_image" | "too_large") {
    super(`photo refused: ${reason}`);
    this.name = "PhotoRefused";
  }
}

/** A HEIC file this browser cannot open is kept as it is: the server turns it. */
export async function shrink(file: Blob): Promise<Shrunk> {
  const picture = await decode(file);
  if (!picture) return keepRaw(file);
  try {
    const size = fit(picture.width, picture.height, LONGEST_EDGE_PX);
    const bytes = await small(picture, size);
    const thumb = await jpeg(draw(picture, fit(picture.width, picture.height, THUMB_EDGE_PX)), 0.7);
    return { bytes, mime: "image/jpeg", width_px: size.width, height_px: size.height, thumb };
  } finally {
    picture.close();
  }
}

export function fit(width: number, height: number, longest: number): { width: number; height: number } {
  const scale = Math.min(1, longest / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

async function decode(file: Blob): Promise<ImageBitmap | null> {
  try {
    return await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch {
    return null;
  }
}

async function keepRaw(file: Blob): Promise<Shrunk> {
  const bytes = await file.arrayBuffer();
  if (!isHeic(bytes)) throw new PhotoRefused("not_an_image");
  if (bytes.byteLength > MOST_BYTES) throw new PhotoRefused("too_large");
  const { width, height } = heicSize(bytes);
  return { bytes, mime: "image/heic", width_px: width, height_px: height, thumb: null };
}

async function small(picture: ImageBitmap, size: { width: number; height: number }): Promise<ArrayBuffer> {
  const canvas = draw(picture, size);
  let bytes = await jpeg(canvas, QUALITIES[0]!);
  for (const quality of QUALITIES.slice(1)) {
    if (bytes.byteLength <= TARGET_BYTES) break;
    bytes = await jpeg(canvas, quality);
  }
  return bytes;
}

function draw(picture: ImageBitmap, size: { width: number; height: number }): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  canvas.width = size.width;
  canvas.height = size.height;
  const pen = canvas.getContext("2d")!;
  pen.fillStyle = "#fff"; // a see-through PNG would otherwise turn black
  pen.fillRect(0, 0, size.width, size.height);
  pen.imageSmoothingQuality = "high";
  pen.drawImage(picture, 0, 0, size.width, size.height);
  return canvas;
}

function jpeg(canvas: HTMLCanvasElement, quality: number): Promise<ArrayBuffer> {
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob.arrayBuffer()) : reject(new PhotoRefused("not_an_image"))), "image/jpeg", quality);
  });
}
