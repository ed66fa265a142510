import { frame, shop, stock } from "../starter-texts.js";

/** One way to be wrong: what is given, how it ends and what it says. */
export interface BadInput {
  readonly name: string;
  /** Files in the working folder that differ from the starter; `undefined` takes a file away. */
  readonly files?: Readonly<Record<string, string | Uint8Array | undefined>>;
  /** `make frame.yaml --out result` when absent. */
  readonly argv?: readonly string[];
  /** 2 when absent. */
  readonly code?: 1 | 2;
  /** Parts of the message, each of which must be there. */
  readonly says: readonly string[];
}

export const starterFiles: Readonly<Record<string, string>> = {
  "frame.yaml": frame,
  "stock.yaml": stock,
  "shop.yaml": shop,
};

export const usualArgv: readonly string[] = ["make", "frame.yaml", "--out", "result"];

/** The frame file with one thing changed. Fails when there is nothing to change, so that no case tests the good file. */
export function frameWith(from: string | RegExp, to: string): { readonly "frame.yaml": string } {
  return { "frame.yaml": changed(frame, from, to) };
}

export function stockWith(from: string | RegExp, to: string): { readonly "stock.yaml": string } {
  return { "stock.yaml": changed(stock, from, to) };
}

export function shopWith(from: string | RegExp, to: string): { readonly "shop.yaml": string } {
  return { "shop.yaml": changed(shop, from, to) };
}

function changed(text: string, from: string | RegExp, to: string): string {
  const result = text.replace(from, () => to);
  if (result === text) throw new Error(`the starter file holds no ${from}`);
  return result;
}
