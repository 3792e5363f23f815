"""What is the shortest way between places, and the best order to visit them in?"""
