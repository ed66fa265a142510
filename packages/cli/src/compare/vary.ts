import { inputError } from "../input/input-error.js";

/** A value of the frame file and what it is to be, one after the other. */
export interface Varied {
  readonly path: string;
  /** As YAML values. */
  readonly values: readonly string[];
}

/** One combination, as `--set` options and by path. */
export interface Combination {
  readonly settings: readonly string[];
  /** In the order of the `--vary` options. */
  readonly values: readonly string[];
}

/** More are no comparison a person reads. */
const mostCombinations = 2000;

/**
 * Reads `--vary path=a,b,c` options. A value may be a range with its step, `50..110:5`, ends included; commas inside
 * brackets, braces and quotes belong to a value.
 *
 * @throws InputError naming the option
 */
export function variedValues(options: readonly string[]): readonly Varied[] {
  const varied = options.map((option): Varied => {
    const shown = `--vary ${option}`;
    const equals = option.indexOf("=");
    const path = option.slice(0, equals).trim();
    if (equals < 0 || path === "") {
      throw inputError(
        shown,
        "write path=values, for example ducts.*.pipe.size=75,110 or deck.length=360..480:20",
      );
    }
    const values = split(option.slice(equals + 1)).flatMap((text) => rangeOrValue(text, shown));
    if (values.some((value) => value === "")) throw inputError(shown, "a value between the commas is empty");
    const twice = values.find((value, index) => values.indexOf(value) !== index);
    if (twice !== undefined) throw inputError(shown, `${twice} is given twice`);
    return { path, values };
  });
  const twice = varied.find(({ path }, index) => varied.findIndex((other) => other.path === path) !== index);
  if (twice !== undefined)
    throw inputError(`--vary ${twice.path}`, "is given twice; put all values in one option");
  const count = varied.reduce((product, { values }) => product * values.length, 1);
  if (count > mostCombinations) {
    throw inputError("--vary", `${count} combinations are more than ${mostCombinations}; give fewer values`);
  }
  return varied;
}

/** Every combination, the last option running fastest. */
export function combinations(varied: readonly Varied[]): readonly Combination[] {
  return varied.reduce<readonly Combination[]>(
    (all, { path, values }) =>
      all.flatMap((before) =>
        values.map((value) => ({
          settings: [...before.settings, `${path}=${value}`],
          values: [...before.values, value],
        })),
      ),
    [{ settings: [], values: [] }],
  );
}

/** At the commas that stand in no bracket, brace or quote. */
function split(text: string): string[] {
  const parts = [""];
  let depth = 0;
  let quote = "";
  for (const letter of text) {
    if (quote !== "") quote = letter === quote ? "" : quote;
    else if (letter === '"' || letter === "'") quote = letter;
    else if ("[{".includes(letter)) depth += 1;
    else if ("]}".includes(letter)) depth -= 1;
    if (letter === "," && depth === 0 && quote === "") parts.push("");
    else parts.push((parts.pop() ?? "") + letter);
  }
  return parts.map((part) => part.trim());
}

const number = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)`;
const range = new RegExp(`^(${number})\\.\\.(${number})(?::(${number}))?$`);

function rangeOrValue(text: string, shown: string): string[] {
  const found = range.exec(text);
  if (found === null) return [text];
  const [from, to, step] = [Number(found[1]), Number(found[2]), Number(found[3] ?? 1)];
  if (!(step > 0)) throw inputError(shown, `a step of ${found[3]} never arrives; give one above 0`);
  const count = Math.floor(Math.abs(to - from) / step + 1e-9) + 1;
  if (count > mostCombinations) throw inputError(shown, `${text} has ${count} values; give a larger step`);
  const way = to < from ? -step : step;
  // Ten decimals take the dust of binary fractions off: 0.1 + 0.2 is 0.3.
  return Array.from({ length: count }, (_, index) => String(Number((from + index * way).toFixed(10))));
}
