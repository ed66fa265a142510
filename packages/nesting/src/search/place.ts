/** A place for an item, and what it costs to lie there. */
export interface Place {
  x: number;
  y: number;
  shape: number;
  box: number;
  cost: number;
}

export function emptyPlace(): Place {
  return { x: 0, y: 0, shape: 0, box: 0, cost: Infinity };
}

export function copyPlace(from: Place, to: Place): void {
  to.x = from.x;
  to.y = from.y;
  to.shape = from.shape;
  to.box = from.box;
  to.cost = from.cost;
}
