import type { Arrangement, Edge } from "./arrangement.js";
import { segmentLength } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";

/** Edges shorter than this (mm) lie wholly within the reach of rounding and of the moves onto nodes: their sides cannot be told. */
const TOO_SHORT = 10 * TOLERANCE;

/**
 * The chosen edges with every edge too short to judge shrunk to a point, whether it was chosen or not. Where three curves pass
 * almost through one point, the judgement of such edges may leave a gap there or a whisker; shrunk, neither remains.
 */
export function contracted(arrangement: Arrangement, chosen: readonly Edge[]): Edge[] {
  const parents = arrangement.nodes.map((_, node) => node);
  const rootOf = (node: number): number => {
    let root = node;
    while (parents[root] !== undefined && parents[root] !== root) root = parents[root] ?? root;
    return root;
  };
  for (const edge of arrangement.edges) {
    if (segmentLength(edge.segment) > TOO_SHORT) continue;
    const [a, b] = [rootOf(edge.from), rootOf(edge.to)];
    parents[Math.max(a, b)] = Math.min(a, b);
  }
  return chosen.flatMap((edge): Edge[] => {
    if (segmentLength(edge.segment) <= TOO_SHORT) return [];
    const [from, to] = [rootOf(edge.from), rootOf(edge.to)];
    const ends = {
      from: arrangement.nodes[from] ?? edge.segment.from,
      to: arrangement.nodes[to] ?? edge.segment.to,
    };
    return [{ ...edge, from, to, segment: { ...edge.segment, ...ends } }];
  });
}
