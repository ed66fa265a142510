import type { LineChange, LineFigures } from "./compare.js";

/** What changed in a line: `1 -> 10 sheet at 98 (was 112)`, `new: 2 pack of 100`. */
export function changeText({ before, after, unit }: LineChange): string {
  if (before === undefined) return `new: ${figuresText(after, unit)}`;
  if (after === undefined) return `no more: ${figuresText(before, unit)}`;
  const quantity =
    before.quantity === after.quantity
      ? `${quantityText(after)} ${unit}`
      : `${quantityText(before)} -> ${quantityText(after)} ${unit}`;
  if ((before.amount === undefined) !== (after.amount === undefined)) {
    return `${quantity}, ${after.amount === undefined ? "which has" : "which had"} no price`;
  }
  if (before.rate === after.rate || before.rate === undefined || after.rate === undefined) {
    return before.quantity === after.quantity ? `the same ${quantity}` : quantity;
  }
  return `${quantity} at ${after.rate} (was ${before.rate})`;
}

function figuresText(figures: LineFigures | undefined, unit: string): string {
  if (figures === undefined) return "";
  if (figures.amount === undefined) return `${quantityText(figures)} ${unit} without a price`;
  const rate = figures.rate === undefined ? "" : ` at ${figures.rate}`;
  return `${quantityText(figures)} ${unit}${rate}`;
}

function quantityText({ quantity }: LineFigures): string {
  return String(Number(quantity.toFixed(2)));
}
