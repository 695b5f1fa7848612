import { describe, expect, it, vi } from 'vitest';
import { createOffline, type Offline } from '../../../src/app/offline';

describe('working without a network', () => {
  it('is ready once the first worker has put everything by, and at once where one serves the page already', async () => {
    const { offline, happens } = await started();
    expect(offline.state()).toBe('none');
    happens('controlling');
    expect(offline.state()).toBe('ready');
    expect((await started({ served: true })).offline.state()).toBe('ready');
  });

  it('says that a newer version waits, and starts it only when told', async () => {
    const { offline, happens, skipped, reload, changes } = await started({ served: true });
    offline.startNewer();
    expect(skipped).not.toHaveBeenCalled();
    happens('waiting');
    expect(offline.state()).toBe('newer');
    expect(changes).toHaveBeenCalledTimes(1);
    expect(reload).not.toHaveBeenCalled();
    offline.startNewer();
    expect(skipped).toHaveBeenCalledTimes(1);
    happens('controlling');
    expect(reload).toHaveBeenCalledTimes(1);
  });

  it('a newer version may come while the page of the first visit is still open', async () => {
    const { offline, happens, reload } = await started();
    happens('controlling');
    happens('waiting');
    offline.startNewer();
    happens('controlling');
    expect(reload).toHaveBeenCalledTimes(1);
  });

  it('a newer version started in another tab does not load this one anew', async () => {
    const { offline, happens, reload } = await started({ served: true });
    happens('waiting');
    happens('controlling');
    expect(reload).not.toHaveBeenCalled();
    expect(offline.state()).toBe('outdated');
    happens('waiting');
    expect(offline.state()).toBe('outdated');
  });

  it('a part that cannot be fetched is told', async () => {
    const { offline, partIsMissing } = await started();
    partIsMissing();
    expect(offline.state()).toBe('outdated');
  });

  it('where a page cannot be put by, nothing is said', async () => {
    const none = createOffline({ worker: () => null, served: false, reload: vi.fn(), nowAndThen: vi.fn(), onMissingPart: vi.fn(), onInstallable: vi.fn() });
    const refused = await started({ register: () => Promise.reject(new DOMException('no', 'SecurityError')) });
    expect([none.state(), refused.offline.state()]).toEqual(['none', 'none']);
  });

  it('lets the browser ask about installing once for each offer, and not without one', async () => {
    const { offline, offer, changes } = await started();
    offline.install();
    const question = vi.fn();
    offer(question);
    expect([offline.canInstall(), changes.mock.calls.length]).toEqual([true, 1]);
    offline.install();
    offline.install();
    expect([offline.canInstall(), question.mock.calls.length, changes.mock.calls.length]).toEqual([false, 1, 2]);
    offer(question);
    offer(null);
    offline.install();
    expect([offline.canInstall(), question.mock.calls.length]).toEqual([false, 1]);
  });

  it('asks for a newer version now and then, and bears having no network', async () => {
    const update = vi.fn(() => Promise.reject(new TypeError('Failed to fetch')));
    const { ask } = await started({ update });
    ask();
    await Promise.resolve();
    expect(update).toHaveBeenCalledTimes(1);
  });
});

async function started({
  served = false,
  register = () => Promise.resolve(undefined),
  update = () => Promise.resolve(),
}: {
  served?: boolean;
  register?: () => Promise<undefined>;
  update?: () => Promise<void>;
} = {}): Promise<{
  offline: Offline;
  happens: (type: 'waiting' | 'controlling') => void;
  skipped: ReturnType<typeof vi.fn>;
  reload: ReturnType<typeof vi.fn>;
  changes: ReturnType<typeof vi.fn>;
  partIsMissing: () => void;
  offer: (question: (() => void) | null) => void;
  ask: () => void;
}> {
  const listeners = new Map<string, (event: never) => void>();
  const [skipped, reload, changes] = [vi.fn(), vi.fn(), vi.fn()];
  const worker = {
    addEventListener: (type: string, listener: (event: never) => void) => void listeners.set(type, listener),
    register,
    update,
    messageSkipWaiting: skipped,
  };
  let partIsMissing = (): void => undefined;
  let ask = (): void => undefined;
  let offer = (_ask: (() => void) | null): void => undefined;
  const offline = createOffline({
    worker: () => Promise.resolve(worker),
    served,
    reload,
    nowAndThen: (run) => (ask = run),
    onMissingPart: (tell) => (partIsMissing = tell),
    onInstallable: (tell) => (offer = tell),
  });
  offline.subscribe(changes);
  await new Promise((done) => setTimeout(done, 0));
  return {
    offline,
    happens: (type) => listeners.get(type)?.({} as never),
    skipped,
    reload,
    changes,
    partIsMissing: () => partIsMissing(),
    offer: (question) => offer(question),
    ask: () => ask(),
  };
}
