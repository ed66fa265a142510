/** Short ways to write DXF and SVG texts by hand. */

type Groups = readonly (readonly [number, string | number])[];

export function dxf(entities: string, { units = 4, blocks = "", layers = "" } = {}): string {
  const header =
    units < 0 ? "" : `0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$INSUNITS\n70\n${units}\n0\nENDSEC\n`;
  const tables =
    layers === "" ? "" : `0\nSECTION\n2\nTABLES\n0\nTABLE\n2\nLAYER\n70\n1\n${layers}0\nENDTAB\n0\nENDSEC\n`;
  const blockSection = blocks === "" ? "" : `0\nSECTION\n2\nBLOCKS\n${blocks}0\nENDSEC\n`;
  return `${header}${tables}${blockSection}0\nSECTION\n2\nENTITIES\n${entities}0\nENDSEC\n0\nEOF\n`;
}

export function entity(type: string, groups: Groups, layer = "0"): string {
  const all: Groups = [[8, layer], ...groups];
  return `0\n${type}\n${all.map(([code, value]) => `${code}\n${value}\n`).join("")}`;
}

export function line(x1: number, y1: number, x2: number, y2: number, layer = "0"): string {
  return entity(
    "LINE",
    [
      [10, x1],
      [20, y1],
      [11, x2],
      [21, y2],
    ],
    layer,
  );
}

export function arc(x: number, y: number, r: number, from: number, to: number, rest: Groups = []): string {
  return entity("ARC", [[10, x], [20, y], [40, r], [50, from], [51, to], ...rest]);
}

export function circle(x: number, y: number, r: number, rest: Groups = [], layer = "0"): string {
  return entity("CIRCLE", [[10, x], [20, y], [40, r], ...rest], layer);
}

type Corner = readonly [x: number, y: number, bulge?: number];

export function lwpolyline(
  corners: readonly Corner[],
  closed = true,
  rest: Groups = [],
  layer = "0",
): string {
  return entity(
    "LWPOLYLINE",
    [
      [90, corners.length],
      [70, closed ? 1 : 0],
      ...rest,
      ...corners.flatMap(
        ([x, y, b = 0]): Groups => [
          [10, x],
          [20, y],
          [42, b],
        ],
      ),
    ],
    layer,
  );
}

export function polyline(corners: readonly Corner[], flags = 1, vertexGroups: Groups = []): string {
  const vertices = corners.map(([x, y, b = 0]) =>
    entity("VERTEX", [[10, x], [20, y], [30, 0], [42, b], ...vertexGroups]),
  );
  return `${entity("POLYLINE", [
    [66, 1],
    [10, 0],
    [20, 0],
    [30, 0],
    [70, flags],
  ])}${vertices.join("")}0\nSEQEND\n8\n0\n`;
}

export function block(
  name: string,
  entities: string,
  base: readonly [number, number] = [0, 0],
  flags = 0,
): string {
  return `0\nBLOCK\n8\n0\n2\n${name}\n70\n${flags}\n10\n${base[0]}\n20\n${base[1]}\n30\n0\n${entities}0\nENDBLK\n8\n0\n`;
}

export function insert(name: string, x: number, y: number, rest: Groups = [], layer = "0"): string {
  return entity("INSERT", [[2, name], [10, x], [20, y], ...rest], layer);
}

export function spline(
  degree: number,
  knots: readonly number[],
  controls: readonly (readonly [number, number])[],
  weights: readonly number[] = [],
): string {
  return entity("SPLINE", [
    [70, 8],
    [71, degree],
    [72, knots.length],
    [73, controls.length],
    [74, 0],
    ...knots.map((knot): [number, number] => [40, knot]),
    ...controls.flatMap(
      ([x, y], index): Groups => [
        [10, x],
        [20, y],
        [30, 0],
        ...(weights[index] === undefined ? [] : [[41, weights[index]] as const]),
      ],
    ),
  ]);
}

export const square = (x: number, y: number, side: number): Corner[] => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];

export function svg(body: string, attributes = 'width="100mm" height="80mm" viewBox="0 0 100 80"'): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${body}</svg>`;
}
