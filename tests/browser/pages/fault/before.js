// What a browser may not have, or not give.
const fault = location.pathname.split('/')[1];
if (fault === 'fault-absent') delete globalThis.WebAssembly;
if (fault === 'fault-canvas') HTMLCanvasElement.prototype.getContext = () => null;
