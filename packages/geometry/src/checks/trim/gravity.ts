/** m/s2, standard gravity (ISO 80000-3). */
export const GRAVITY = 9.80665;
