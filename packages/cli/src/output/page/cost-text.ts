import type { CostEstimate } from "../../cost/cost-estimate.js";
import { type Money, moneyText } from "../../cost/money.js";

type Currency = Pick<CostEstimate, "currency" | "exponent">;

/** Minor units as a figure without its currency: `1 234.50`. */
export function costText(money: Money, { exponent }: Currency): string {
  const [whole = "0", fraction] = moneyText(Math.abs(money), exponent).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, "\u202F");
  return `${money < 0 ? "\u2212" : ""}${grouped}${fraction === undefined ? "" : `.${fraction}`}`;
}

/** The same with the currency code after it. */
export function costWithCurrency(money: Money, currency: Currency): string {
  return `${costText(money, currency)}\u00A0${currency.currency}`;
}
