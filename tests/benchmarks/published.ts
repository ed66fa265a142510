/**
 * Best and average densities, in percent, of 10 runs of 20 minutes and more: A. Elkeran, "A new approach for sheet
 * nesting problem using guided cuckoo search and pairwise clustering", European Journal of Operational Research 231
 * (2013) 757-769. The figures are from memory; a few hundredths are noise. The jigsaws are full by construction.
 */
export const published: Readonly<Record<string, { readonly best: number; readonly average?: number }>> = {
  albano: { best: 89.58, average: 87.47 },
  blaz: { best: 84.84, average: 82.4 },
  dagli: { best: 89.51, average: 87.06 },
  fu: { best: 92.41, average: 90.68 },
  shapes0: { best: 68.79, average: 67.26 },
  shapes1: { best: 76.73, average: 73.79 },
  shirts: { best: 88.96, average: 87.59 },
  swim: { best: 75.94, average: 74.49 },
  trousers: { best: 91.0, average: 89.02 },
  dighe1: { best: 100 },
  dighe2: { best: 100 },
};
