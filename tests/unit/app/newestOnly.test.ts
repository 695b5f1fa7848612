import { expect, test } from 'vitest';
import { newestOnly } from '../../../src/app/newestOnly';

test('one question at a time, and of those that wait the newest; the others are told that they were passed over', async () => {
  const asked: number[] = [];
  const answers: (() => void)[] = [];
  const ask = newestOnly((question: number) => {
    asked.push(question);
    return new Promise<string>((resolve) => answers.push(() => resolve(`answer ${question}`)));
  });
  const [first, second, third] = [ask(1), ask(2), ask(3)];
  expect(asked).toEqual([1]);
  expect(await second).toBeNull();
  answers[0]!();
  expect(await first).toBe('answer 1');
  await Promise.resolve();
  expect(asked).toEqual([1, 3]);
  answers[1]!();
  expect(await third).toBe('answer 3');
  await Promise.resolve();
  const fourth = ask(4);
  answers[2]!();
  expect(await fourth).toBe('answer 4');
});
