import type { StudyOptions } from "@startgap/study";
import { later } from "../scripts/inModules.ts";
import { handOver, slugOf } from "../state/files.ts";
import { isCurrent, type Session, type SessionStore, type Shown } from "../state/session.ts";
import type { LaterAnswer } from "../study/laterMessages.ts";
import { longWork } from "../study/longWork.ts";

/** A report is about the cabinet as it stands, with the delay that was tried where there is one. */
function askedOf({ delay_s, shown }: Session): { shown: Shown; options: StudyOptions; stem: string } | null {
  if (shown === null) return null;
  return { shown, options: delay_s === null ? {} : { delay_s }, stem: slugOf(shown.cabinet.title) };
}

async function offer(
  store: SessionStore,
  what: string,
  make: (asked: NonNullable<ReturnType<typeof askedOf>>) => Promise<Blob | { failed: string }>,
  ending: string,
): Promise<void> {
  const session = store.get();
  const asked = askedOf(session);
  if (asked === null || !isCurrent(session)) {
    store.set({
      notice: `The ${what} can be made once the cabinet can be run: put right what is marked first.`,
    });
    return;
  }
  store.set({ notice: `Making the ${what} …` });
  const made = await make(asked).catch((error: Error) => ({ failed: `${error.message}.` }));
  if ("failed" in made) return store.set({ notice: `The ${what} could not be made. ${made.failed}` });
  const name = `${asked.stem}${ending}`;
  handOver(made, name);
  store.set({ notice: `Saved as ${name}.` });
}

const sentenceOf = (answer: LaterAnswer | null): string =>
  answer?.say === "failed" ? answer.sentence : "It was stopped.";

/** Everything that an inspector asks for, in one file that stands alone. */
export const offerReport = (store: SessionStore): Promise<void> =>
  offer(
    store,
    "report",
    async ({ shown: { cabinet }, options, stem }) => {
      const answer = await longWork({ ask: "everything", cabinet, options }).answer;
      if (answer?.say !== "everything") return { failed: sentenceOf(answer) };
      const { check, beside } = answer;
      const { reportOf } = await later();
      const fileName = `${stem}.cabinet.json`;
      const text = reportOf({ ...beside, cabinet, check, options, fileName });
      return new Blob([text], { type: "text/html" });
    },
    ".report.html",
  );

/** Every curve of every case, for a spreadsheet. */
export const offerTable = (store: SessionStore): Promise<void> =>
  offer(
    store,
    "table of curves",
    async ({ shown: { cabinet }, options }) => {
      const answer = await longWork({ ask: "table", cabinet, options }).answer;
      if (answer?.say !== "table") return { failed: sentenceOf(answer) };
      return new Blob([answer.text], { type: "text/csv" });
    },
    ".curves.csv",
  );
