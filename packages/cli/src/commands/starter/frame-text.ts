import { type StarterChoice, usualChoice } from "./choices.js";

/** Length of every duct's pipe, mm. */
const ductLength = 120;

/** Where ducts stand and how long the deck is, mm. */
interface StarterLayout {
  readonly deck: number;
  readonly ducts: readonly {
    readonly id: string;
    readonly axis: string;
    readonly x: number;
    readonly y: number;
  }[];
}

/** A first frame file: every line a beginner needs, nothing more. Lengths in it are millimetres. */
export function starterFrame(choice: StarterChoice): string {
  const { motor, material } = choice;
  const layout = layOut(choice);
  return `# A frame: everything keelcut derives plates, hardware and costs from.
# All lengths are millimetres. x points forward, y to port, z up; the middle of the deck's top is 0, 0, 0.
# What is not written here takes a default; \`keelcut schema frame\` lists every value with its meaning.
keelcut: 1
name: Starter
stock: stock.yaml      # sheets, pipes and hardware with their prices
shop: shop.yaml        # how plates are cut and what that costs

sheets:
  structure: {material: ${material}, thickness: 10}   # cheeks and deck
  carrier: {material: PVC-U, thickness: 5}      # the plates that hold the motors

# A duct is a pipe with a motor inside. surge pushes forward, heave pushes up.
# Sizes of pipe are in the built-in tables: keelcut catalog
# Once you know the propeller, add it to its duct, propeller: {diameter: 60, height: 12}: then its room is checked, and it is
# among the parts to buy.
ducts:
${ductLines(layout, choice)}
# cross: two holes on each of two circles at 90 degrees; also {circle: 25, holes: 4} and {rectangle: [31, 31]}.
motors:
  outrunner:
    pattern: ${motor.pattern}
    screw: ${motor.screw}
    body: {diameter: ${motor.diameter}, length: ${motor.length}}
    threadDepth: ${motor.threadDepth}       # a longer screw would reach the winding
    # mass: 75           # with its propeller, g; without it nobody can tell whether the vehicle floats level

rods: {thread: M6}
# nuts: lock                # lock nuts at the ends of rods and screws; rods and screws get as much longer

deck:
  length: ${layout.deck}
`;
}

/** The frame file of the usual choice. */
export const frameText: string = starterFrame(usualChoice);

/** Surge ducts side by side a pipe's width off the middle; heave ducts before and behind them, clear of both. */
function layOut({ pipe, ducts }: StarterChoice): StarterLayout {
  const aside = Math.ceil(pipe.outside / 5) * 5;
  const pair = (x: number): StarterLayout["ducts"] => [
    { id: "port", axis: "surge", x, y: aside },
    { id: "starboard", axis: "surge", x, y: -aside },
  ];
  if (ducts === 2) return { deck: 300, ducts: pair(-40) };
  // Half a surge duct, air, and half a heave duct.
  const apart = Math.ceil((ductLength / 2 + 15 + pipe.outside / 2) / 5) * 5;
  // From the farthest middle to the deck's end: half a duct with its cable ties, and an edge.
  const end = Math.max(pipe.outside / 2 + 25, ductLength / 2);
  const tens = (length: number): number => Math.ceil(length / 10) * 10;
  if (ducts === 3) {
    const x = Math.round(apart / 2);
    return {
      deck: tens(Math.max(300, apart + 2 * end)),
      ducts: [...pair(-x), { id: "heave", axis: "heave", x: apart - x, y: 0 }],
    };
  }
  return {
    deck: tens(2 * (apart + end)),
    ducts: [
      ...pair(0),
      { id: "bow", axis: "heave", x: apart, y: 0 },
      { id: "stern", axis: "heave", x: -apart, y: 0 },
    ],
  };
}

function ductLines(layout: StarterLayout, { pipe }: StarterChoice): string {
  const series = pipe.series === undefined ? "" : `, series: ${pipe.series}`;
  return layout.ducts
    .map(
      ({ id, axis, x, y }) => `  - id: ${id}
    axis: ${axis}
    at: [${x}, ${y}]
    pipe: {standard: ${pipe.standard}, size: ${pipe.size}${series}}
    length: ${ductLength}
    motor: outrunner
`,
    )
    .join("");
}
