export { writeDimensioned } from "./dimensioned/write-dimensioned.js";
export { type Paper, papers, tilingOf } from "./tiles.js";
export { writePdf } from "./write-pdf.js";
