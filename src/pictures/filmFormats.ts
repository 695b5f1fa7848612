/** What films this browser can write, asked of its encoders (WebCodecs) without fetching anything. */
import { SOUND_RATE } from './toneSamples';

export interface FilmFormat {
  readonly container: 'mp4' | 'webm';
  readonly video: 'avc' | 'vp9' | 'vp8';
  /** Null where this browser has no encoder for a sound that goes with it. */
  readonly sound: 'aac' | 'opus' | null;
}

/**
 * Formats for a size, the one that most players open first. MP4 with H.264 is that where its sound can be AAC; where only Opus can be had, which
 * fewer players expect in an MP4, WebM comes first. Empty where there is no encoder.
 */
export async function filmFormats(widthPx: number, heightPx: number): Promise<FilmFormat[]> {
  if (typeof VideoEncoder === 'undefined') return [];
  const size = { width: widthPx, height: heightPx };
  const [avc, vp9, vp8, aac, opus] = await Promise.all([
    writesVideo({ ...size, codec: 'avc1.640028' }),
    writesVideo({ ...size, codec: 'vp09.00.40.08' }),
    writesVideo({ ...size, codec: 'vp8' }),
    writesSound('mp4a.40.2'),
    writesSound('opus'),
  ]);
  const formats: FilmFormat[] = [];
  if (vp9 || vp8) formats.push({ container: 'webm', video: vp9 ? 'vp9' : 'vp8', sound: opus ? 'opus' : null });
  if (avc) formats[aac ? 'unshift' : 'push']({ container: 'mp4', video: 'avc', sound: aac ? 'aac' : opus ? 'opus' : null });
  return formats;
}

/** A browser that cannot even read the question cannot write it. */
const writesVideo = (config: VideoEncoderConfig): Promise<boolean> =>
  VideoEncoder.isConfigSupported(config).then(({ supported }) => supported === true, () => false);

async function writesSound(codec: string): Promise<boolean> {
  if (typeof AudioEncoder === 'undefined') return false;
  return AudioEncoder.isConfigSupported({ codec, sampleRate: SOUND_RATE, numberOfChannels: 1 }).then(({ supported }) => supported === true, () => false);
}
