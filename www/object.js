// What of what comes from outside has fields.

/** @param {any} value */
export const isObject = value => typeof value === 'object' && value !== null && !Array.isArray(value);
