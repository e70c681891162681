import { JUDGED } from "../../record/office/kept.ts";
import { logFound } from "../../record/office/log-found.ts";
import { findingOf } from "../examine-log.ts";
import type { Book } from "./book.ts";
import { derivedRows } from "./derive.ts";
import { type SentRows, sentRows } from "./sent.ts";
import { visitOf } from "./settle.ts";
import { inTransaction, replaceRows } from "./write.ts";

/** Visits in a transaction. */
const PAGE = 100;

/** How many visits an older program has judged. */
export async function staleVisits({ db }: Book): Promise<number> {
  const { count } = await db
    .selectFrom("visits")
    .select((of) => of.fn.countAll<string>().as("count"))
    .where("judged", "<", JUDGED)
    .executeTakeFirstOrThrow();
  return Number(count);
}

interface Stale {
  readonly revision: string;
  readonly revisions: number;
  readonly forked: boolean;
  readonly bundle: string;
}

async function sentAnew({ bundle, revision, revisions, forked }: Stale): Promise<SentRows> {
  const visit = visitOf(bundle);
  const rows = derivedRows(visit, revision, logFound(await findingOf(visit)));
  return sentRows({ ...rows, visits: rows.visits.map((row) => ({ ...row, revisions, forked })) });
}

/**
 * Judges those visits anew, each from its revision that stands; gives back how many. What was done stays where it is
 * stopped, and goes on the next time. Throws a `Trouble` where a kept revision is no sound bundle.
 * @param now ISO 8601
 */
export async function judgeAnew({ db }: Book, now: () => string, stopped: () => boolean): Promise<number> {
  let all = 0;
  while (!stopped()) {
    const done = await inTransaction(db, now(), async (tx) => {
      const stale = await tx
        .selectFrom("visits")
        .innerJoin("revisions", (join) =>
          join.onRef("revisions.visit_id", "=", "visits.visit_id").onRef("digest", "=", "revision"),
        )
        .select(["visits.visit_id", "revision", "revisions", "forked", "bundle"])
        .where("judged", "<", JUDGED)
        .limit(PAGE)
        .execute();
      await replaceRows(
        tx,
        stale.map(({ visit_id }) => visit_id),
        await Promise.all(stale.map(sentAnew)),
      );
      return stale.length;
    });
    all += done;
    if (done < PAGE) break;
  }
  return all;
}
