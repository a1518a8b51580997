/**
 * The trench as a building block: its section, the stone and fabric in it, what is hauled away and
 * put back, whether soil, fabric, stone and pipe suit one another, and what a metre costs at a
 * depth. It knows no route.
 *
 * <p>{@link org.yardfall.trench.MetrePrice} turns a {@link org.yardfall.trench.TrenchSection} and
 * the user's unit prices into the price of a metre; the search for a route weighs with it and the
 * bill is written with it, so the two agree by construction.
 */
package org.yardfall.trench;
