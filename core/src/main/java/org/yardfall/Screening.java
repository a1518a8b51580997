package org.yardfall;

import org.yardfall.site.Site;

/** The whole job in one call. */
public final class Screening {

  private final Site site;

  private Screening(Site site) {
    this.site = site;
  }

  /** A screening of the given site. */
  public static Screening of(Site site) {
    return new Screening(site);
  }

  /** The site that is screened. */
  public Site site() {
    return site;
  }
}
