/** Questions that are put faster than they are answered: one at a time, and of those that wait only the newest. */

/** The one that is asked; `null` for a question in whose place a newer one was put. `ask` is not to reject. */
export function newestOnly<Question, Answer>(ask: (question: Question) => Promise<Answer>): (question: Question) => Promise<Answer | null> {
  let isBusy = false;
  let waiting: { readonly question: Question; readonly answer: (answer: Answer | null) => void } | null = null;
  const run = async (question: Question, answer: (answer: Answer) => void): Promise<void> => {
    isBusy = true;
    answer(await ask(question));
    isBusy = false;
    const next = waiting;
    waiting = null;
    if (next !== null) await run(next.question, next.answer);
  };
  return (question) =>
    new Promise((answer) => {
      if (isBusy) {
        waiting?.answer(null);
        waiting = { question, answer };
      } else void run(question, answer);
    });
}
