/** Imported before all else, by a test in a browser's clothes: the app then speaks French. */
localStorage.setItem('fellmark-language', 'fr');
