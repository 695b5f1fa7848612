/** Makes messages ready as the page is built: a plugin of both passes, and of the workers in each. */
import { IntlMessageFormat } from 'intl-messageformat';
import { type Plugin, transformWithOxc } from 'vite';
import { isSimple } from '../src/words/messageFormat.ts';

/**
 * Messages are parsed as the page is built, and the parser stays behind: half of what intl-messageformat weighs. In development they are
 * parsed in the page. What is simple stays text.
 */
export function parsedMessages(): Plugin {
  return {
    name: 'parsed-messages',
    apply: 'build',
    config: () => ({ resolve: { alias: [{ find: /^@formatjs\/icu-messageformat-parser$/, replacement: '@formatjs/icu-messageformat-parser/no-parser.js' }] } }),
    async transform(source, id) {
      if (!/\/src\/words\/(en|de)\/\w+\.ts$/.test(id)) return null;
      const { code } = await transformWithOxc(source, id);
      const areas = (await import(`data:text/javascript,${encodeURIComponent(code)}`)) as Record<string, Record<string, string>>;
      const parsed = Object.entries(areas).map(([area, messages]) => {
        const each = Object.entries(messages).map(([key, message]) => [key, parsedMessage(message)]);
        return `export const ${area} = ${JSON.stringify(Object.fromEntries(each))};`;
      });
      return { code: parsed.join('\n'), map: null, moduleType: 'js' };
    },
  };
}

const parsedMessage = (message: string): unknown =>
  isSimple(message) ? message : new IntlMessageFormat(message, 'en', undefined, { ignoreTag: true }).getAst();
