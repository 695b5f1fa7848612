import react from '@vitejs/plugin-react';
import { type Plugin, defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { parsedMessages } from './build/parsedMessages.ts';
import { oneFile } from './build/oneFile.ts';

/**
 * React and what the small state library needs stay together in the first load, so that neither the 3D part nor the
 * notation can drag a copy or a neighbour of theirs into it; those two have chunks of their own, fetched when shown.
 */
const libraryChunks = [
  { name: 'react', test: /node_modules\/(react|react-dom|scheduler|zustand|use-sync-external-store)\//, priority: 3 },
  { name: 'three', test: /node_modules\/(three|@react-three|its-fine|suspend-react|react-use-measure)\//, priority: 2 },
  { name: 'vexflow', test: /node_modules\/vexflow\//, priority: 1 },
  // In the first load and in later parts too: in one piece they take 1 kB less (gzip) than in the many that the parts would cut them into.
  {
    name: 'shared',
    test: /src\/(core\/(?!findings|monteCarlo|drawnBands|random|tryOut|predictAt|mouthMoves|fileNames)|notebook\/(Choice|NumberField|numberText|noteNames|Moving|entry|focusHeading|kept\/AskOnce|kept\/words)|print\/sheetText|app\/(history|idle|measuringDoor|classDoor|besideDoor|SessionContext|RecordsContext|FallBack|capabilities|describe|useEntry|useStageProps|localDay))[\w/]*\.tsx?$/,
    priority: 1,
  },
];

export default defineConfig({
  // Relative by default: the built app runs from any folder of any server. RIMPATH_BASE sets a fixed one.
  base: process.env['RIMPATH_BASE'] ?? './',
  plugins: [react(), contentSecurityPolicy(), parsedMessages(), oneFile(), offline()],
  server: { host: '127.0.0.1' },
  preview: { host: '127.0.0.1' },
  worker: { format: 'es', plugins: () => [parsedMessages()] },
  build: {
    outDir: 'dist',
    target: 'es2022',
    // kB before gzip; the 3D library alone is larger than the default of 500.
    chunkSizeWarningLimit: 1200,
    rolldownOptions: { output: { codeSplitting: { groups: libraryChunks } } },
  },
});

/** The published page may load only what lies beside it. Not in development, where the server writes scripts into the page. */
function contentSecurityPolicy(): Plugin {
  const policy = [
    "default-src 'self'",
    // The notation and the graphics set styles on what they draw.
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self' data:",
    "worker-src 'self' blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return {
    name: 'content-security-policy',
    apply: 'build',
    transformIndexHtml: () => [
      { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: policy }, injectTo: 'head-prepend' },
    ],
  };
}

/**
 * Everything the app may need is put by at the first visit, so that it opens and works without a network. A newer version waits until
 * the person says so (src/app/offline.ts) or all pages of the older one are closed; it never takes over in the middle of a lesson.
 */
function offline(): ReturnType<typeof VitePWA> {
  return VitePWA({
    registerType: 'prompt',
    injectRegister: false,
    manifest: {
      id: './',
      name: 'Rimpath',
      short_name: 'Rimpath',
      description: 'From the travel of a brass player’s rim over the teeth to the swing of the horn.',
      lang: 'en',
      start_url: './',
      scope: './',
      display: 'standalone',
      background_color: '#FBF8F3',
      theme_color: '#1D2330',
      icons: [
        { src: './icons/icon-192.png', sizes: '192x192', type: 'image/png' },
        { src: './icons/icon-512.png', sizes: '512x512', type: 'image/png' },
        { src: './icons/icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
      ],
    },
    workbox: {
      globPatterns: ['**/*.{html,js,css,woff2,svg,png}'],
      // The first page is served by it as well: parts that are fetched when shown are then there without a network.
      clientsClaim: true,
      // Bytes before compression; the page saved as one file holds everything and is larger than the default of 2 MiB.
      maximumFileSizeToCacheInBytes: 8 * 1024 * 1024,
    },
  });
}
