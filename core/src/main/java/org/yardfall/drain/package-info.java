/**
 * A route made buildable.
 *
 * <p>{@link org.yardfall.drain.DrainCatchmentFinder} finds the ground whose water the drain takes,
 * stretch by stretch, along the flow field. From it the flow accumulates along the lines, branches
 * into the lines that they join, the pipe of every stretch is chosen, and the hydraulic grade line
 * is drawn from the outlet's water upstream. {@link org.yardfall.drain.TakeOff} counts what it
 * takes to build and prices it with the same {@link org.yardfall.trench.MetrePrice} that the search
 * weighed with. {@link org.yardfall.drain.Caution} tells what to mind, each with its station and
 * number.
 */
package org.yardfall.drain;
