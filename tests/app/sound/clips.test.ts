import { describe, expect, test } from "vitest";
import { FIRST_SETTINGS, type Settings } from "../../../src/app/settings.ts";
import { Clips } from "../../../src/app/sound/clips.ts";
import type { Clip } from "../../../src/device/clips/clip.ts";
import type { ClipRow, ClipShelf } from "../../../src/device/notebook/clip-shelf.ts";
import type { Entry } from "../../../src/visit/entry.ts";
import { entries } from "../build.ts";

const SOUND = new Float32Array(4);
const CLIP: Clip = { type: "audio/ogg; codecs=opus", data: new ArrayBuffer(4) };
const NOW = "2026-11-25T08:00:00.000Z";

const entry = (seq: number): Entry => {
  const [made] = entries({ kind: "note", text: "" });
  if (!made) throw new Error("Expected an entry.");
  return { ...made, seq };
};

/** Clips over a shelf in memory, an encoder and a player that end when the test says so. */
function keeping(change: Partial<Settings> = {}) {
  const world = { settings: { ...FIRST_SETTINGS, ...change }, stored: undefined as unknown, full: false };
  const rows: ClipRow[] = [];
  const done: string[] = [];
  const ends: { encode: (clip: Clip) => void; play: (error?: Error) => void } = {
    encode: () => {},
    play: () => {},
  };
  const shelf: ClipShelf = {
    async keep(row, key, allows) {
      if (world.full) throw new Error("disk full");
      const allowed = allows(world.stored);
      done.push(`${key} ${allowed ? "allow" : "refuse"}`);
      if (allowed) rows.push(row);
      return allowed;
    },
    of: async (visitId) => rows.filter((row) => row.visitId === visitId).map(({ seq }) => seq),
    get: async (visitId, seq) => rows.find((row) => row.visitId === visitId && row.seq === seq) ?? null,
    async dropBefore(at) {
      done.push(`drop before ${at}`);
      if (world.full) throw new Error("disk full");
      rows.splice(0);
      return 0;
    },
    dropAll: async () => {},
    keepAll: async () => {
      throw new Error("What is said is kept one by one.");
    },
    rowsOf: async (visitId) => rows.filter((row) => row.visitId === visitId),
    count: async () => rows.length,
  };
  const clips = new Clips({
    shelf,
    encoder: {
      prepare: () => done.push("prepared"),
      encode: () =>
        new Promise((resolve) => {
          done.push("encoding");
          ends.encode = resolve;
        }),
    },
    player: {
      play: () =>
        new Promise((resolve, reject) => {
          done.push("playing");
          ends.play = (error) => (error ? reject(error) : resolve());
        }),
      stop: () => ends.play(),
    },
    settings: () => world.settings,
    settingsKey: "settings",
    now: () => NOW,
    sounds: async (sounding) => {
      done.push("deaf");
      await sounding().finally(() => done.push("hears"));
    },
    reason: (error) => (error instanceof Error ? error.message : "?"),
  });
  const settle = () => new Promise<void>((resolve) => setImmediate(resolve));
  /** Keeps sound in the open visit, whole. */
  const kept = async (seq: number, visitId = "v1") => {
    const keep = clips.keep(visitId, entry(seq), SOUND);
    ends.encode(CLIP);
    await keep;
  };
  return { clips, world, rows, done, ends, settle, kept };
}

describe("keeping", () => {
  test("sound is encoded, then stored with the place and the time of its entry, and offered", async () => {
    const { clips, rows, done, kept } = keeping();
    await clips.open("v1");
    await kept(3);
    expect(rows).toEqual([{ visitId: "v1", seq: 3, at: entry(3).at, ...CLIP }]);
    expect([...clips.kept.value]).toEqual([3]);
    expect(done).toEqual(["encoding", "settings allow"]);
  });
  test("who speaks is kept with it, where that was chosen", async () => {
    const { rows, kept } = keeping({ speaker: "p1" });
    await kept(0);
    expect(rows).toEqual([{ visitId: "v1", seq: 0, at: entry(0).at, ...CLIP, speaker: "p1" }]);
  });
  test("switched off, it is not even encoded", async () => {
    const { clips, rows, done } = keeping({ keepClips: false });
    await clips.keep("v1", entry(0), SOUND);
    clips.prepare();
    expect([rows, done]).toEqual([[], []]);
  });
  test("switched off while it was encoded, it is not stored", async () => {
    const { clips, world, rows, ends } = keeping();
    await clips.open("v1");
    const keep = clips.keep("v1", entry(0), SOUND);
    world.stored = { ...FIRST_SETTINGS, keepClips: false };
    ends.encode(CLIP);
    await keep;
    expect([rows, clips.kept.value.size]).toEqual([[], 0]);
  });
  test("where it cannot be stored, one sentence says so", async () => {
    const { clips, world, kept } = keeping();
    world.full = true;
    await kept(0);
    expect(clips.trouble.value).toBe("The sound of the last words was not kept: disk full.");
    world.full = false;
    await kept(1);
    expect(clips.trouble.value).toBeNull();
  });
  test("that comes late, of another visit, is stored there and not offered here", async () => {
    const { clips, rows, kept } = keeping();
    await clips.open("v2");
    await kept(0, "v1");
    expect([rows.length, clips.kept.value.size]).toEqual([1, 0]);
    await clips.open("v1");
    expect([...clips.kept.value]).toEqual([0]);
  });
});

describe("playing", () => {
  test("the ear is deaf meanwhile, and the place of what plays is known", async () => {
    const { clips, done, ends, settle, kept } = keeping();
    await clips.open("v1");
    await kept(2);
    done.length = 0;
    const play = clips.play(2);
    await settle();
    expect([clips.playing.value, done]).toEqual([2, ["deaf", "playing"]]);
    ends.play();
    await play;
    expect([clips.playing.value, done.at(-1)]).toEqual([null, "hears"]);
  });
  test("stopped, the ear hears again", async () => {
    const { clips, done, settle, kept } = keeping();
    await clips.open("v1");
    await kept(2);
    const play = clips.play(2);
    await settle();
    clips.stop();
    await play;
    expect([clips.playing.value, done.at(-1)]).toEqual([null, "hears"]);
  });
  test("a sound that is gone plays nothing and is offered no more", async () => {
    const { clips, rows, done, kept } = keeping();
    await clips.open("v1");
    await kept(2);
    rows.splice(0);
    await clips.play(2);
    expect(done).not.toContain("playing");
    expect(clips.kept.value.size).toBe(0);
  });
  test("a sound that the browser cannot play is told", async () => {
    const { clips, ends, settle, kept } = keeping();
    await clips.open("v1");
    await kept(2);
    const play = clips.play(2);
    await settle();
    ends.play(new Error("this browser cannot play it"));
    await play;
    expect(clips.trouble.value).toBe("The sound cannot be played: this browser cannot play it.");
    expect(clips.playing.value).toBeNull();
  });
});

describe("deleting in time", () => {
  test.each([
    [7, "2026-11-18T08:00:00.000Z"],
    [30, "2026-10-26T08:00:00.000Z"],
    [90, "2026-08-27T08:00:00.000Z"],
  ] as const)("%d days back from now is %s", async (clipDays, before) => {
    const { clips, done, kept } = keeping({ clipDays });
    await clips.open("v1");
    await kept(0);
    await clips.expire();
    expect(done.at(-1)).toBe(`drop before ${before}`);
    expect(clips.kept.value.size).toBe(0);
  });
  test("where it fails, one sentence says so", async () => {
    const { clips, world } = keeping();
    world.full = true;
    await clips.expire();
    expect(clips.trouble.value).toBe("Old sound could not be deleted: disk full.");
  });
});
