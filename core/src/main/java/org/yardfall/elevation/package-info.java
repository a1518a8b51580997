/**
 * The ground as a grid of elevations in metres: rasters read by window, survey shots triangulated.
 *
 * <p>How a raster becomes ground. {@link org.yardfall.elevation.RasterFiles} tells a GeoTIFF from
 * an ASCII grid by its first bytes and reads its header: where the cells lie, in which CRS, how a
 * cell is stored, what marks an unknown one, in which unit elevations are. What cannot be
 * elevations is refused here. {@link org.yardfall.elevation.AlignedRasters} lays rasters of one
 * grid together, turns stored values into metres and unknown cells into NaN; {@link
 * org.yardfall.elevation.GroundLayer} knows where they lie on the working plane. Where the cells
 * are square and north-up in the working CRS they are handed on to the bit; else {@link
 * org.yardfall.elevation.Resampler} interpolates. {@link org.yardfall.elevation.Seams} watches for
 * steps between rasters, {@link org.yardfall.elevation.GroundSense} for numbers that are no ground.
 * {@link org.yardfall.elevation.ElevationSource} is the way in.
 *
 * <p>How shots become ground. {@link org.yardfall.elevation.ShotFile} reads them: encoding ({@link
 * org.yardfall.elevation.TextFile}), delimiter and decimal sign ({@link
 * org.yardfall.elevation.ShotDialect}), order of columns ({@link
 * org.yardfall.elevation.ShotColumns}, held against where the shots should lie) and a sieve for
 * single shots that cannot be right ({@link org.yardfall.elevation.ShotSieve}). {@link
 * org.yardfall.elevation.ShotSurface} makes one shot of those in one place, takes out blunders
 * ({@link org.yardfall.elevation.BlunderFinder}), joins breaklines by field code ({@link
 * org.yardfall.elevation.FieldCodes}), nodes them ({@link org.yardfall.elevation.Breaklines}) and
 * triangulates ({@link org.yardfall.elevation.Triangulator}); outlets and house corners among the
 * shots become the site's ({@link org.yardfall.elevation.SurveyedFeatures}); LandXML may bring its
 * own triangles ({@link org.yardfall.elevation.LandXmlShots}); of a point cloud the ground points
 * are taken, thinned where they are very many ({@link org.yardfall.elevation.PointCloud}). The
 * {@link org.yardfall.elevation.Tin} knows the ground between the shots and nothing beyond them.
 * Where there is a raster too, {@link org.yardfall.elevation.RasterTie} says how the shots stand
 * off it and, where asked, moves and bends it to them. {@link org.yardfall.elevation.Contours}
 * draws lines of one elevation.
 */
package org.yardfall.elevation;
