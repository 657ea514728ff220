// What a page has by name before any other script.
document.names = Object.getOwnPropertyNames(globalThis);
