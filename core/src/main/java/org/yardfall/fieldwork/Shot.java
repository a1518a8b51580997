package org.yardfall.fieldwork;

/**
 * A point shot in the yard.
 *
 * @param id its number or name; text from outside
 * @param x x in metres of the working plane
 * @param y y in metres of the working plane
 * @param zM elevation in metres of the plan's vertical datum
 * @param code its field code, or empty; text from outside
 */
public record Shot(String id, double x, double y, double zM, String code) {}
