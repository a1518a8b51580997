/** What a pipe carries and takes in; knows no route. */
package org.yardfall.pipe;
