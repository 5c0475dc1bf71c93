/** Why a ride broke off. @param at of its own time, s */
export const brokeOffWords = (at: number): string => `no next step at ${at.toFixed(1)} s`;
