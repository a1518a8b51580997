/** Results as map layers in open formats. */
package org.yardfall.layer;
