/** What stands in everything that leaves a book of invented data, such as the demonstration: the one sentence of it. */
export const INVENTED = "Invented data: a demonstration, nothing of it was measured.";
