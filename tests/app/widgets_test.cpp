// Filled by the commit that brings what it tests.
