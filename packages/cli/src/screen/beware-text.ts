import type { Frame } from "@keelcut/geometry";
import { chooseCautions } from "../output/page/index.js";
import { painted } from "./colour.js";
import type { Screen } from "./screen.js";
import { wrapped } from "./wrapped.js";

/** The titles of the cautions that a job calls for. */
export function bewareText(frame: Frame, screen: Screen, width: number): string {
  const titles = chooseCautions({ frame, plates: frame.plates }).map((caution) => caution.title);
  return wrapped(`${painted("Beware", "bold", screen.colour)} ${titles.join("; ")}.`, width, "  ");
}
