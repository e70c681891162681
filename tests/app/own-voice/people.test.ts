import "fake-indexeddb/auto";
import { describe, expect, test } from "vitest";
import { activeVoice } from "../../../src/app/own-voice/active-voice.ts";
import { People } from "../../../src/app/own-voice/people.ts";
import { exportVoice } from "../../../src/app/own-voice/voice-file.ts";
import { READERS } from "../../../src/app/readers.ts";
import { FIRST_SETTINGS, type Settings } from "../../../src/app/settings.ts";
import { type Notebook, openNotebook } from "../../../src/device/notebook/notebook.ts";
import type { VoiceProfile } from "../../../src/device/spotter/voice-profile.ts";
import { BASE, brief, voiceOf, voiceWithPhones } from "./voices.ts";

let notebooks = 0;

/** The people of a device with a notebook of its own. */
async function device(voices: readonly VoiceProfile[] = [], speaker: string | null = null) {
  notebooks += 1;
  const notebook = await openNotebook(READERS, null, `people-${notebooks}`);
  for (const voice of voices) await notebook.voices.keep(voice);
  let settings: Settings = { ...FIRST_SETTINGS, speaker };
  const problems: string[] = [];
  let ids = 0;
  const people = new People({
    voices: notebook.voices,
    settings: () => settings,
    changeSettings: async (change) => {
      settings = { ...settings, ...change };
    },
    guard: async (work) => {
      try {
        await work();
        return true;
      } catch (error) {
        problems.push(String(error));
        return false;
      }
    },
    newId: () => {
      ids += 1;
      return `new-${ids}`;
    },
    base: async () => BASE,
    readBytes: async (file) => new Uint8Array(await file.arrayBuffer()),
  });
  await people.load();
  const names = () => people.voices.value.map(({ name }) => name);
  return { notebook, people, names, problems, speaker: () => settings.speaker };
}

const file = (voice: VoiceProfile) => new File([exportVoice(voice)], "voice.json");
const ADA = voiceOf();
const BEN = voiceOf({ id: "p2", name: "Ben" });

describe("several people share a device", () => {
  test("they are listed by name, with all that was learned", async () => {
    const { people, names } = await device([BEN, ADA]);
    expect(names()).toEqual(["Ada Quill", "Ben"]);
    expect(brief(people.find("p1"))).toEqual(brief(ADA));
  });

  test("who was taught speaks from then on; taught again, the new one is in the place of the old", async () => {
    const { people, names, speaker } = await device([BEN], "p2");
    await people.keep(ADA);
    expect([names(), speaker()]).toEqual([["Ada Quill", "Ben"], "p1"]);
    await people.keep({ ...ADA, name: "Ada", gain: { heldBack: 4, rightBefore: 1, rightAfter: 2 } });
    expect(names()).toEqual(["Ada", "Ben"]);
  });

  test("taught again, what was learned of phrases stays", async () => {
    const { people } = await device([{ ...voiceWithPhones(), ...ADA }]);
    await people.keep({ ...ADA, name: "Ada" });
    expect(people.find("p1")?.name).toBe("Ada");
    expect(people.find("p1")?.phones?.phrases).toBe(40);
  });

  test("switched after another window has deleted it, it does not come back; nor is lost what that one learned", async () => {
    const { people, notebook } = await device([ADA, BEN]);
    await notebook.voices.drop("p2");
    await people.switch("p2", false);
    expect(await notebook.voices.get("p2")).toBe(undefined);
    await notebook.voices.keep({ ...voiceWithPhones(), ...ADA });
    await people.switch("p1", false);
    expect(people.find("p1")).toMatchObject({ on: false, phones: { phrases: 40 } });
  });

  test("one that is switched off stays, and is not used", async () => {
    const { people, notebook, names } = await device([ADA], "p1");
    expect(brief(await activeVoice(notebook, "p1"))).toEqual(brief(ADA));
    await people.switch("p1", false);
    expect([names(), await activeVoice(notebook, "p1")]).toEqual([["Ada Quill"], null]);
    await people.switch("p1", true);
    expect(brief(await activeVoice(notebook, "p1"))).toEqual(brief(ADA));
  });

  test("one tap deletes, from the disk too, and one more brings it back as it was", async () => {
    const { people, notebook, names, speaker } = await device([ADA, BEN], "p1");
    await people.remove("p1");
    expect([names(), speaker()]).toEqual([["Ben"], null]);
    expect(brief(await notebook.voices.all())).toEqual(brief([BEN]));
    await people.undo();
    expect(brief(people.find("p1"))).toEqual(brief(ADA));
    expect([people.dropped.value, speaker()]).toEqual([null, "p1"]);
  });

  test.each([
    ["somebody else spoke", "p2", "p2"],
    ["nobody in particular spoke", null, null],
  ])("deleted and brought back while %s, they go on speaking", async (_, before, after) => {
    const { people, speaker } = await device([ADA, BEN], before);
    await people.remove("p1");
    await people.undo();
    expect(speaker()).toBe(after);
  });

  test("brought back, it speaks again if it did, unless somebody else was chosen since", async () => {
    const { people, speaker } = await device([ADA, BEN], "p1");
    await people.remove("p1");
    expect(speaker()).toBe(null);
    await people.undo();
    expect(speaker()).toBe("p1");
    await people.remove("p1");
    await people.choose("p2");
    await people.undo();
    expect(speaker()).toBe("p2");
    await people.remove("p1");
    await people.undo();
    expect(speaker()).toBe("p2");
  });

  test("what was deleted before is not brought back by undoing the last", async () => {
    const { people, names } = await device([ADA, BEN]);
    await people.remove("p1");
    await people.remove("p2");
    await people.undo();
    expect(names()).toEqual(["Ben"]);
  });
});

describe("who speaks now", () => {
  test.each([
    ["nobody in particular", null],
    ["somebody who is not here any more", "gone"],
  ])("%s: the shipped ear", async (_, speaker) => {
    const { notebook } = await device([ADA], speaker);
    expect(await activeVoice(notebook, speaker)).toBeNull();
  });

  test("a profile that was damaged on the disk is not used, is told, and can be deleted", async () => {
    const short = { ...ADA.spotter.head, bias: new Float32Array(3) };
    const { people, notebook, names } = await device([
      { ...ADA, spotter: { ...ADA.spotter, head: short } },
      BEN,
    ]);
    expect([names(), people.damaged.value]).toEqual([["Ben"], ["p1"]]);
    expect(await activeVoice(notebook, "p1")).toBeNull();
    await people.remove("p1");
    expect(people.damaged.value).toEqual([]);
    expect(brief(await notebook.voices.all())).toEqual(brief([BEN]));
  });

  test("one that was taught to another ear is told", async () => {
    const { people } = await device([BEN]);
    expect(people.fits(ADA)).toBe(true);
    expect(people.fits({ spotter: { ...ADA.spotter, base: "o".repeat(43) } })).toBe(false);
  });
});

describe("a voice from a file", () => {
  test("comes to another device whole, under an id of its own there", async () => {
    const { people, notebook } = await device([BEN]);
    await people.bringIn(file({ ...ADA, on: false }));
    expect(people.broughtIn.value).toEqual({
      kept: true,
      sentences: ['The voice of "Ada Quill" is here now: choose it under “Who speaks now” to use it.'],
    });
    expect(brief(await notebook.voices.get("new-1"))).toEqual(brief({ ...ADA, id: "new-1" }));
  });

  const older = { ...ADA, spotter: { ...ADA.spotter, base: "o".repeat(43) } };
  test.each<[string, File, string]>([
    ["the same again", file({ ...BEN, id: "p9" }), 'The voice of "Ben" is here already.'],
    ["of an older ear", file(older), 'The voice of "Ada Quill" was taught to an older ear: teach it again.'],
    ["no voice", new File(["[]"], "x.json"), "Expected an object {…}, found a list."],
    [
      "too large",
      new File([" ".repeat(2_200_000)], "x.json"),
      "Expected a voice file of at most 2 MiB, found 2.1 MiB.",
    ],
  ])("%s: refused in a sentence, and nothing changes", async (_, given, sentence) => {
    const { people, notebook } = await device([BEN]);
    await people.bringIn(given);
    expect(people.broughtIn.value).toEqual({ kept: false, sentences: [sentence] });
    expect(brief(await notebook.voices.all())).toEqual(brief([BEN]));
  });
});

test("what the notebook does not take is told, and the list stays", async () => {
  const { people, names, problems, notebook } = await device([ADA]);
  const failing: Notebook["voices"] = {
    ...notebook.voices,
    drop: () => Promise.reject(new Error("no disk")),
  };
  const broken = new People({
    voices: failing,
    settings: () => FIRST_SETTINGS,
    changeSettings: async () => {},
    guard: async (work) => {
      try {
        await work();
        return true;
      } catch (error) {
        problems.push(String(error));
        return false;
      }
    },
    newId: () => "x",
    base: async () => BASE,
    readBytes: async () => new Uint8Array(),
  });
  await broken.load();
  await broken.remove("p1");
  expect(problems).toEqual(["Error: no disk"]);
  expect(broken.dropped.value).toBeNull();
  await people.load();
  expect(names()).toEqual(["Ada Quill"]);
});
