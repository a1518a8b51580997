/**
 * Results as pages for people; draws what is there and computes nothing anew.
 *
 * <p>On the terminal {@link org.yardfall.sheet.SummaryText}: what the water does, what to build and
 * why, what to mind. On paper {@link org.yardfall.sheet.PlanSheet}: the plan to scale with the
 * legend of what is drawn on it, then profiles, then in columns cautions, reasons, pipe,
 * quantities, points, crossings and what was assumed. In a browser {@link
 * org.yardfall.sheet.ReviewPage}. For a neighbour or an authority {@link
 * org.yardfall.sheet.EvidencePage}: the ground alone, without any drain.
 *
 * <p>The stages say their sentences in metres; {@code Wording} restates them in the reader's units.
 * What holds for the whole drain is said once on each page ({@code Cautions}), what was assumed is
 * grouped by what it is about and where it comes from ({@code AssumedNotes}).
 */
package org.yardfall.sheet;
