/** What either worker answers when it cannot. */
export interface Failed {
  readonly say: "failed";
  readonly sentence: string;
}

/** A mistake in the study must not leave the page waiting. */
export function caught<Question, Answer>(
  answerTo: (question: Question) => Answer,
  question: Question,
): Answer | Failed {
  try {
    return answerTo(question);
  } catch (error) {
    const sentence = `The study stopped: ${error instanceof Error ? error.message : error}.`;
    return { say: "failed", sentence };
  }
}
