package org.yardfall;

import java.util.List;
import java.util.Optional;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Site;
import org.yardfall.water.DammedWater;
import org.yardfall.water.LevelledGround;
import org.yardfall.water.LevelledGround.Swale;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;
import org.yardfall.water.SwaleLeveller;

/**
 * A site with its ground as it will be, and the water there.
 *
 * @param site the site
 * @param terrain the ground, swales that are to be levelled being filled
 * @param water its surface water
 * @param levelled the ground before and after, where swales are levelled
 */
record ShapedSite(
    Site site, Terrain terrain, SurfaceWater water, Optional<LevelledGround> levelled) {

  /** The site on its ground as it is, shaped as the user asks. */
  static ShapedSite of(Site site, Terrain terrain, SurfaceWater water) {
    if (site.levelled().isEmpty()) {
      return new ShapedSite(site, terrain, water, Optional.empty());
    }
    LevelledGround levelled = SwaleLeveller.level(terrain, water, site);
    SurfaceWater after = SurfaceWaterFinder.find(levelled.after(), site);
    return new ShapedSite(site, levelled.after(), after, Optional.of(levelled));
  }

  /** The same site as its ground is now. */
  ShapedSite now() {
    return levelled
        .map(l -> new ShapedSite(site, l.before(), l.waterBefore(), Optional.empty()))
        .orElse(this);
  }

  /** What that does to the water of neighbours, in words. */
  List<String> warnings() {
    return levelled.map(l -> DammedWater.on(site, l, water)).orElse(List.of());
  }

  /** The swales that are levelled. */
  List<Swale> swales() {
    return levelled.map(LevelledGround::swales).orElse(List.of());
  }
}
