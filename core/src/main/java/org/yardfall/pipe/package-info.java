/**
 * The pipe as a building block: what generic pipes carry, full and part full; what gets into them
 * through fabric, stone and openings; how high water stands in them; how long water takes to leave;
 * what groundwater adds. It knows no route.
 *
 * <p>Flow is uniform by {@link org.yardfall.pipe.Manning}, and gradually varied along {@link
 * org.yardfall.pipe.HydraulicGradeLine}, which starts at the water outside the outlet. Pipes come
 * from {@link org.yardfall.pipe.PipeTable}.
 */
package org.yardfall.pipe;
