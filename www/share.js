// How a mean of marks is told: of the refresher, of a class, of a lesson in a learning system.

/** A share from 0 to 1 in whole hundredths, a half as the next above; one that does not pass `mark` stands below it, however near it comes. @param {number} share @param {number} [mark] */
export const hundredths = (share, mark = Infinity) => Math.min(Math.round(share * 100), Math.max(0, Math.round(mark * 100) - 1));

/** The same in per cent. @param {number} share @param {number} [mark] */
export const percent = (share, mark) => `${hundredths(share, mark)}\u202f%`;
