package org.yardfall.water;

import java.util.List;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Assumption;

/**
 * The ground as the water sees it.
 *
 * @param ground buildings stand in it, openings are cut through it
 * @param roofs where the roofs' water comes down
 * @param altered the cells that openings lowered, opening by opening, upstream to downstream
 * @param assumptions what was assumed
 * @param warnings what was odd, in words
 */
record ShapedGround(
    ElevationGrid ground,
    RoofRunoff roofs,
    List<AlteredCell> altered,
    List<Assumption> assumptions,
    List<String> warnings) {}
