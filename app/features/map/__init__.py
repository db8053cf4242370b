"""Stance map: full cant over binding angle and stance length."""
