import PDFDocument from "pdfkit";

/** A document without pages yet, and its bytes once it is ended: the same for the same content, whenever it is made. */
export interface NewPdf {
  readonly document: PDFKit.PDFDocument;
  readonly bytes: Promise<Uint8Array>;
}

export function newPdf(title: string): NewPdf {
  const document = new PDFDocument({
    autoFirstPage: false,
    info: { Title: title, CreationDate: new Date(0), Producer: "Keelcut", Creator: "Keelcut" },
  });
  const parts: Uint8Array[] = [];
  const bytes = new Promise<Uint8Array>((resolve, reject) => {
    document.on("data", (part: Uint8Array) => parts.push(part));
    document.on("end", () => resolve(Buffer.concat(parts)));
    document.on("error", reject);
  });
  return { document, bytes };
}
