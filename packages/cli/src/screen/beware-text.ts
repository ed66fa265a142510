import { isHeld } from "../job/bridges.js";
import type { Job } from "../job/job.js";
import { chooseCautions } from "../output/page/index.js";
import { painted } from "./colour.js";
import type { Screen } from "./screen.js";
import { wrapped } from "./wrapped.js";

/** The titles of the cautions that a job calls for. */
export function bewareText({ frame, input }: Job, screen: Screen, width: number): string {
  const held = isHeld(frame.plates, input.shop);
  const titles = chooseCautions({ frame, plates: frame.plates, held }).map((caution) => caution.title);
  return wrapped(`${painted("Beware", "bold", screen.colour)} ${titles.join("; ")}.`, width, "  ");
}
