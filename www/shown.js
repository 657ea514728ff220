// Questions of kinds that put no rig in a figure themselves, out of their lesson.

/**
 * Shows the rig of a question of a kind that puts none itself in a figure of its own, its forces held back until it is marked.
 * @param {HTMLElement & { asked?: any }} question @param {any} figure
 */
export function shown(question, figure) {
  figure.setAttribute('veiled', '');
  const put = () => {
    if (question.asked) figure.rig = question.asked.rig();
    else if (figure.isConnected) requestAnimationFrame(put);
  };
  figure.addEventListener('outlean-ready', put, { once: true });
  question.addEventListener('outlean-marked', () => {
    put();
    figure.reveal();
  });
}
