package org.yardfall.site;

/**
 * Something that was not given and was therefore assumed; listed with every result.
 *
 * @param about the site-file key or the quantity concerned, for example {@code drain.min-grade}
 * @param value what was assumed, with its unit
 * @param source where the assumed value comes from: a publication, a file, or {@code common
 *     practice, no source}
 */
public record Assumption(String about, String value, String source) {}
