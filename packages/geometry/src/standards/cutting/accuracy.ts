/**
 * How far a cut edge may lie from its drawn place, mm, where neither frame nor shop says better. Common practice of routers,
 * lasers and water jets on plates of some hundred millimetres; ISO 2768-1 class f allows 0.1 on 6 to 30 mm, 0.15 on 30 to
 * 120. A shop that promises class m only (0.2, 0.3) should be written into the shop profile.
 */
export const usualAccuracy = 0.1;
