/** What has to be known of threads where none is started: Node's own module for them takes its time to load. */

export const mostJobs = 64;

/** The program's first word where it is started as a thread. */
export const threadWord = "--as-a-thread";
