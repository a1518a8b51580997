package org.yardfall.site;

import java.util.OptionalDouble;
import org.locationtech.jts.geom.Polygon;

/**
 * A building's footprint.
 *
 * @param id its id; text from outside
 * @param outline its footprint in metres of the working plane, valid
 * @param footingBottomM elevation of the underside of its footing in metres, where known
 */
public record Building(String id, Polygon outline, OptionalDouble footingBottomM) {}
