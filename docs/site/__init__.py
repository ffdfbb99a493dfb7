"""The pages of the documentation site, made from the program, its data and its written pages.

    python -m docs.site FOLDER      write the Markdown of every page there

``make site`` has Sphinx turn them into the site. Nothing made here is kept in the project.
"""
