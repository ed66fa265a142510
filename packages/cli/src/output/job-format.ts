/** Name of the job record in an output folder. */
export const jobFileName = "job.json";

/** First field of a job record: by it an output folder is known as ours. */
export const jobFormat = "keelcut-job";

/** Raised when a reader of older records could misunderstand a new one. */
export const jobVersion = 1;
