/** Whether this is the built program: from sources no thread can be started, and nothing that the build makes lies beside. */
export const built = import.meta.url.endsWith(".js");
