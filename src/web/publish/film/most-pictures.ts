/** An archive has room for some 65 000 files and 4 GB; a picture of an overlay has a tenth of a megabyte. */
export const MOST_PICTURES = 30_000;
