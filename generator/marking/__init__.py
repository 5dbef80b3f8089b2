"""What the person wrote -> its value -> a verdict, with the slip named."""
