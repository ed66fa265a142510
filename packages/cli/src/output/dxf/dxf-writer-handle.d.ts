/** The counter behind the handles of dxf-writer, which has no types of its own. */
declare module "dxf-writer/src/Handle.js" {
  const Handle: { seed: number };
  export default Handle;
}
