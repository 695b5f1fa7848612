/** For Node that loads the tests' modules itself, without a bundler: tsx reads TypeScript, and what only a bundler understands is made plain. */
import 'tsx';
import { register } from 'node:module';

register('./nativeHooks.mjs', import.meta.url);
