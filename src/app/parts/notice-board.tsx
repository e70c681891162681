import type { Workplace } from "../workplace.ts";

/** What just happened or went wrong, a sentence a line. */
export function NoticeBoard({ workplace }: { readonly workplace: Workplace }) {
  const notice = workplace.notice.value;
  if (!notice) return null;
  return (
    <div class={`notice notice-${notice.kind}`} role={notice.kind === "problem" ? "alert" : "status"}>
      <ul>
        {notice.sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <button
        type="button"
        class="plain"
        onClick={() => {
          workplace.notice.value = null;
        }}
      >
        Close
      </button>
    </div>
  );
}
