package org.yardfall.fieldwork;

/**
 * One check of a laid pipe.
 *
 * @param name what was checked: {@code level, line, adverse grade, belly, missing cover, complete,
 *     shots agree}
 * @param passed whether it holds everywhere
 * @param worstM the worst value met in metres; NaN where nothing was met
 * @param limitM the limit it was held against in metres
 * @param at where the worst is, in words with the shot's name; may be empty
 */
public record ProofCheck(String name, boolean passed, double worstM, double limitM, String at) {}
