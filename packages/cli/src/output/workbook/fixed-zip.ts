/** 1 January 1980, the first day a ZIP entry can bear: no time of writing gets into the file. */
const FIXED_DATE = 0x0021;
const CENTRAL_ENTRY = 0x02014b50;
const LOCAL_ENTRY = 0x04034b50;
const END_RECORD = 0x06054b50;

/**
 * The same ZIP file with every entry dated 1 January 1980, so that equal content gives equal bytes. Dates are outside the
 * checksums (PKWARE APPNOTE, sections 4.3.7 and 4.3.12). Throws when the bytes are no plain ZIP file.
 */
export function withFixedDates(zip: Uint8Array): Uint8Array {
  const bytes = zip.slice();
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endRecord(view);
  let entry = view.getUint32(end + 16, true);
  for (let count = view.getUint16(end + 10, true); count > 0; count--) {
    if (view.getUint32(entry, true) !== CENTRAL_ENTRY) throw new Error("not a ZIP directory");
    setDate(view, entry + 12);
    const local = view.getUint32(entry + 42, true);
    if (view.getUint32(local, true) !== LOCAL_ENTRY) throw new Error("not a ZIP entry");
    setDate(view, local + 10);
    const lengths = [28, 30, 32].map((at) => view.getUint16(entry + at, true));
    entry += 46 + lengths.reduce((sum, length) => sum + length, 0);
  }
  return bytes;
}

function setDate(view: DataView, at: number): void {
  view.setUint16(at, 0, true);
  view.setUint16(at + 2, FIXED_DATE, true);
}

function endRecord(view: DataView): number {
  for (let at = view.byteLength - 22; at >= 0; at--) {
    if (view.getUint32(at, true) === END_RECORD) return at;
  }
  throw new Error("not a ZIP file");
}
