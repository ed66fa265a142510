import { expect, it } from "vitest";
import { compileInstance, withDemand } from "../../../packages/nesting/src/search/instance.js";
import { hooks } from "../strip/small-strips.js";

it("an instance with other numbers of copies is what compiling it anew gives", () => {
  const compiled = (demand: readonly number[]) =>
    compileInstance(
      hooks.items.map(({ polygon, rotations }, k) => ({
        polygon,
        demand: demand[k] as number,
        turns: (rotations as readonly number[]).map((rotation) => ({ rotation, mirrored: false })),
      })),
      [],
      { height: hooks.height },
    );
  const one = compiled([1, 1, 1, 1]);
  for (const demand of [
    [3, 0, 2, 7],
    [0, 5, 0, 0],
  ]) {
    const own = withDemand(one, demand);
    expect(own).toEqual(compiled(demand));
    expect(own.pairs).toBe(one.pairs);
  }
});
