// Nothing of its own: what is compiled with it is the precompiled header of the tests.
