"""What every report is made with."""
