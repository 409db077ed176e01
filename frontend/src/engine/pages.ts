/** Draws the pages of a PDF as pictures. Nothing in it is run or followed: no scripts, no links, no addresses. */
import type { PDFDocumentProxy } from "pdfjs-dist";
import { PAGES } from "../sync/enginefiles.ts";

export interface Pages {
  /** In points, as they are seen, turned pages turned. */
  sizes: { width_pt: number; height_pt: number }[];
  draw: (page: number, canvas: HTMLCanvasElement, width_px: number) => Promise<void>;
  close: () => void;
}

/** `locked`: it asks for a password. `damaged`: it cannot be read. `absent`: what draws it could not be had now. */
export class NotDrawn extends Error {
  constructor(readonly reason: "locked" | "damaged" | "absent") {
    super(`not drawn: ${reason}`);
    this.name = "NotDrawn";
  }
}

const SHARP = 2; // more dots than two for each of the screen's cost memory and show nothing

export async function openPages(bytes: ArrayBuffer): Promise<Pages> {
  const { getDocument, GlobalWorkerOptions } = await drawer();
  GlobalWorkerOptions.workerSrc = `${PAGES}pdf.worker.min.mjs`;
  // A copy: the worker takes the bytes for itself.
  const loading = getDocument({ data: new Uint8Array(bytes.slice(0)), useWasm: false, enableXfa: false });
  try {
    const pdf = await loading.promise;
    const close = () => void loading.destroy();
    return { sizes: await sizesOf(pdf), draw: (page, canvas, width_px) => draw(pdf, page, canvas, width_px), close };
  } catch (error) {
    void loading.destroy();
    throw new NotDrawn((error as Error).name === "PasswordException" ? "locked" : "damaged");
  }
}

async function drawer(): Promise<typeof import("pdfjs-dist")> {
  try {
    return (await import(/* @vite-ignore */ `${PAGES}pdf.min.mjs`)) as typeof import("pdfjs-dist");
  } catch {
    throw new NotDrawn("absent");
  }
}

async function sizesOf(pdf: PDFDocumentProxy): Promise<Pages["sizes"]> {
  const sizes = [];
  for (let page = 1; page <= pdf.numPages; page += 1) {
    const { width, height } = (await pdf.getPage(page)).getViewport({ scale: 1 });
    sizes.push({ width_pt: width, height_pt: height });
  }
  return sizes;
}

async function draw(pdf: PDFDocumentProxy, number: number, canvas: HTMLCanvasElement, width_px: number): Promise<void> {
  const page = await pdf.getPage(number);
  const dots = width_px * Math.min(devicePixelRatio, SHARP);
  const viewport = page.getViewport({ scale: dots / page.getViewport({ scale: 1 }).width });
  canvas.width = Math.floor(viewport.width);
  canvas.height = Math.floor(viewport.height);
  await page.render({ canvas, viewport }).promise;
  page.cleanup();
}
